"""Quilt booklets from one pattern file: read, size, plan, draw, publish.

The subpackages are the pipeline, in the order in which data flows through them:
``reading``, ``sizing``, ``planning``, ``booklet``, ``drawing``, ``publishing``, ``site``.
:mod:`seamleaf.api` holds what programs of one's own need of it.
``lengths`` is the exact arithmetic under all of them.
"""
