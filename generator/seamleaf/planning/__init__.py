"""Quilt to the cutting, piecing, pressing, joining and finishing of its booklet."""
