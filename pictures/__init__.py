"""The pictures of the README, and what draws them."""
