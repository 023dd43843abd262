"""What a build shows of each pattern: its pages, pictures and PDF files, kept for the next build."""
