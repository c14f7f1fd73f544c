"""What the rules found, as text, JSON, JUnit, SARIF and tables for the sheets."""
