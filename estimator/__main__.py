"""``python -m estimator``: the command line, for launchers and for shells that do not find ``kerfledger``."""

from estimator.cli import main

if __name__ == "__main__":
    main()
