"""shopset: one YAML spec of a built-in wall in, its complete set of shop drawings out."""

__version__ = "0.1.0"
__all__ = ["__version__"]
