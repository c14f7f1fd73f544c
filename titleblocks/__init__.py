"""Title blocks, borders and sheet sizes as YAML: data that ships with the package."""
