"""Bending strips and sheets: how long they must be, where and how far to bend them."""
