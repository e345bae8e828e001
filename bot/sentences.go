package bot

// The sentences of the conversation itself, in one place. They follow the rules
// of speech of package wording: terse, warm, the words of the trade.
const (
	hello     = "I figure pipe offsets: how long to cut the piece, and where. Text me as you would a mate:"
	helloMore = "help tells the rest."

	// help fits one phone screen: 20 lines of 40 letters.
	help = `Tell me two of set, run, travel and angle, and the pipe:
10 set 45s 2 pvc
roll 9 rise 12 45s 2 copper
set 14 in 30 of room, 2 pvc
26 center to center, 90s, 3/4 copper
18 ft at 1/4 per ft, 2 abs
16-15/16 - 3

After an answer:
same but 14 · with 22s · in abs
takeoff 1-1/8 (yours, kept)
explain · cautions · undo
call it laundry · jobs

Yours: takeoffs · forget takeoff 1 ·
forget me · metric on · handbook two ·
thirty seconds on · spanish`

	welcome = "Any time."

	nothingToChange  = "There is nothing to change yet. Tell me the whole of it, like: 10 set 45s 2 pvc"
	nothingToExplain = "There is nothing to explain yet. Ask me for a cut first."
	nothingToUndo    = "There is no job to drop."
	nothingToCancel  = "Nothing is waiting."
	canceled         = "Dropped."

	noJobs      = "No jobs yet."
	earlierJobs = "(%d earlier)"
	noSuchJob   = "There is no job %d; jobs lists them."
	noJobToName = "There is no such job to name. Ask me for a cut first."
	callItWhat  = "Call it what? Like: call it laundry"
	dropped     = "Dropped %s"

	takeoffOfWhat     = "Takeoff of which fitting? Like: my 2 pvc 45s are 1-1/8 takeoff"
	takeoffOfWhichEnd = "The ends differ: %s and %s. Say which one, like: my 2 pvc 45s are 1-1/8 takeoff"
	faceLessDepth     = "That is %s to the face, less %s that the pipe goes in (%s)."
	asYouSaid         = "as you said"
	noTakeoffs        = "None of your own yet. Measure a fitting and tell me: my 2 pvc 45s are 1-1/8 takeoff"
	howToForget       = "To drop one: forget takeoff 1"
	noSuchTakeoff     = "You have no such takeoff; takeoffs lists yours."
	forgotten         = "Forgotten: %s"
	forgetWhat        = "Forget what? A takeoff (forget takeoff 1), a job (forget job 3), or all of it (forget me)."
	allForgotten      = "All that I kept of yours is gone: jobs, takeoffs, settings."

	metricOn        = "Millimeters first from now on."
	metricOff       = "Inches first from now on."
	handbookTwo     = "Handbook figures from now on: multipliers to two decimals. exact turns it off."
	handbookThree   = "Handbook figures from now on: multipliers to three decimals. exact turns it off."
	handbookOff     = "Exact figures from now on."
	inEnglish       = "English from now on."
	inSpanish       = "De ahora en adelante, en español."
	inSixteenths    = "Sixteenths from now on."
	inThirtySeconds = "Thirty-seconds from now on."
	noSuchSetting   = "I have no such setting. help lists them."

	noDrawing = "I don't draw. explain gives the figuring step by step."
)
