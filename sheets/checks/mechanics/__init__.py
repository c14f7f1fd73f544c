"""What several rules reckon with: strength, movement, sag, what touches what, which value decides."""
