"""Is the bill right: one small check per file, each giving findings as data."""
