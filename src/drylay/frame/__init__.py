"""Members put under every line, end and joint: rims, joists, noggins, splices."""
