"""The same pure functions over very many sets, players, conditions and candidates, on one machine or on many.

A study is cut into blocks, each reckoned alone from its number. `engine.sweep` hands blocks in chunks to workers, keeps
every finished chunk in a folder, and adds the blocks up along one fixed tree.
"""
