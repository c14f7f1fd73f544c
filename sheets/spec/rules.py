def broken_rules(spec, source):
    return ()
