"""Annotated Doc -> Draft: what was said, sorted into procedures."""
