"""Plane geometry in millimetres, over shapely: for rooms that lay out what is no rectangle."""
