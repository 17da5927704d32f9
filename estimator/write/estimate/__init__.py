"""The priced workbook: formulas with the engine's values stored beside them, so that it re-prices itself."""
