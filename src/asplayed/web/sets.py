"""Take in: a list in anybody's words, read as it is typed, its questions answered in place, and stored."""

routes = ()
