"""Shapes to SVG and to paper at true size; charts."""
