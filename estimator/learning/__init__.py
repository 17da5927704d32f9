"""How sure a quote is, and what the shop's own log says of the handbook. Pure: no files, no money."""
