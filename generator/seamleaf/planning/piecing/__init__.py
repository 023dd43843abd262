"""Block trees to units in sewing order: what each takes, its seams, its method and its sizes."""
