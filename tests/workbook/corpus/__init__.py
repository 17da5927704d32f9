"""Invented cut lists, messy as real ones are: one trap each, every customer, mark and job made up."""
