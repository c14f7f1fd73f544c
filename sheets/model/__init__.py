"""What is built: parts, materials, joints, stations, features and the wall they make.

Types only. Resolve fills them; checks, schedules and views read them; nothing here computes or draws.
"""
