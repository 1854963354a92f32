"""The plan: noun, JSON codec, schema, reasons by path, measures, diff."""
