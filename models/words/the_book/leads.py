"""Sentences that lead from one thing to the next in the book."""

ASSUMED = "These sizes are assumed. Measure yours and put them into the job before you cut anything."
TEST_FIRST = "Cut the first joint in scrap. It says more about the set-up than any square."
NO_FINISH = (
    "The job gives no finished thickness, so there are no figures here. Plane both faces alike, and at least the tips "
    "away."
)
NO_SAMPLE = (
    "No bend test is worked out: the job names no wood with figures, or nothing is known of so steep a slope. Prove a "
    "sample all the same before the boat depends on the joint."
)
NOTHING_FOUND = "Nothing found that needs care"
NOT_HERE = "made by another run: not in this folder"
