"""The words of pages and figures: catalogues of texts by key, one file a language."""

from seamleaf.words.catalogue import Text, WordingError, Words, english, form_of, placeholders, read_texts
from seamleaf.words.direction import isolated

__all__ = ["Text", "WordingError", "Words", "english", "form_of", "isolated", "placeholders", "read_texts"]
