"""The commands: each names its files, calls one task, prints what it found and chooses the exit code."""
