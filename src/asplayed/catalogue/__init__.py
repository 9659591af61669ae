"""Published parts: what makers say, when each was offered, and which part a list means."""
