"""Recording -> annotated Doc: the words of the trade found in what was said."""
