"""Short pages: choosing boards, planing the glued stick, proving a sample. Uses drawing, planing, strength, words."""
