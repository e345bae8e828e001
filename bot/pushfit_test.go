package bot_test

import "testing"

// Of a ring seal it is told how far the pipe goes in and how far it is drawn back,
// with a cut and without: the depths are those of EN 1329-1 and EN 1451-1 as recalled,
// 62 mm at 110. Where the lengths are declared by who makes the fitting, no cut is
// made up: 424.26 - 2 × 44 - 2 × 10 = 316.26.
func TestPushFitTellsDepthAndGap(t *testing.T) {
	h := juniperStreet(t)
	h.say("set 300 mm 45s 110 mm pvc", "Travel 424 mm", "No cut yet", "own z")
	h.say("why", "draw it back 10 mm in each seal", "It goes in about 62 mm to the stop (EN 1329-1 and EN 1451-1, as I recall it)")
	h.say("44", "Cut about 316 mm", "Draw back 10 mm in each seal")
	h.say("why", "draw it back 10 mm in each seal", "It goes in about 62 mm to the stop")
	h.say("takeoff for a 110 mm pp 45", "own measure, z", "It goes in about 62 mm")
	h.say("what is an expansion gap?", "drawn back in a ring seal")
	h.say("what is insertion?", "How far the pipe goes into the fitting")
}
