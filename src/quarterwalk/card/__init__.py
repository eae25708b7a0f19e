"""The walk card: where to stop, what to count and what counts come to, for a phone to take along.

The phone compares counts with the card's tables; it computes nothing. Every table is taken
from the core's own rules.
"""

from quarterwalk.card.about import CardFor, LastCall
from quarterwalk.card.check import CardFault, check_card
from quarterwalk.card.make import Card, card_hash, make_card

__all__ = ["Card", "CardFault", "CardFor", "LastCall", "card_hash", "check_card", "make_card"]
