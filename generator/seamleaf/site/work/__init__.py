"""The sizes of patterns worked out and proved: on processes here or many machines, and the same thing never twice."""
