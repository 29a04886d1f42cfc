"""From a job to a request for a plan, from the plan to plain numbers: the room that knows both plan and sled."""
