"""How fast the estimate is, as ratios within one run; not a timed test. Run: ``python -m scripts.bench [--quick]``."""
