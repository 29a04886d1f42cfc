"""The cut along the sled: ways to end it, knife and guard, feed, balance, order of work, scene. Uses sled."""
