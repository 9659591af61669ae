"""Choosing: what-ifs beside today's set, the best settings of one club, and the best set, proven."""
