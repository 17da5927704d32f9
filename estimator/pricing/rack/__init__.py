"""The rack against a job: what is in each cylinder, how hard each tip pulls, what each line leaves, what to order."""
