"""kerfledger: costing and estimating for shops that cut steel with an oxy-fuel torch."""

__version__ = "0.1.0"
