"""Physics: pure, vectorised functions of plain numbers and arrays. No files, no money, no table look-ups."""
