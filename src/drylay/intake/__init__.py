"""How anything written by people gets in: TOML with its places, and keys read one by one."""
