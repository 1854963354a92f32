"""How boards lie on an outline: fields, rows, borders, breaker boards, pieces as they are sawn."""
