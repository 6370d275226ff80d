"""A draft written out, one format a module; `registry.py` lists them."""
