"""Jobs made for tests: invented lists priced with the invented example shop."""
