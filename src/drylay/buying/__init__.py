"""Order lines, packs, money and proof."""
