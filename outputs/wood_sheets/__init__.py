"""Short pages about the wood: choosing boards, planing the glued stick, proving a sample joint."""
