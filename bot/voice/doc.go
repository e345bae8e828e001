// Package voice hears: a voice note in, guesses at what was said out. Nothing
// leaves the machine.
//
// A note is read by [Read]: Ogg with Opus, which is what phones send, or WAV. It
// is decoded in Go, to 16,000 samples a second, and limited in length before it
// is decoded whole.
//
// An [Ear] listens to the sound. The one here is [Pocketsphinx], Debian's
// recognizer, run as a process for each note: the program stays free of C, a
// note that makes the recognizer crash or hang takes nothing else with it, and
// loading it costs a few hundredths of a second, which a process kept warm would
// not be worth. It hears by a dictionary and a language model of the trade,
// which the command in the folder teach makes of the parser's vocabulary and of
// the corpus of messages. Another engine needs a type with the one method.
//
// # Two decoders, many guesses
//
// Each note is decoded twice, as it is and with its noise taken off, and each
// decoder gives its likeliest guesses with how far each lies behind the first.
// Which guess is right is not for this package: it knows nothing of pipe. Two
// decoders that differ, or a near second guess that means something else, are
// what tells the caller to ask rather than to answer.
//
// # Caveats
//
// The model is of American English and of this trade. It hears requests best;
// everyday words are in it, marked with a ~, so that other talk is not forced
// into one, and numbers that are read out have words of their own. It will
// mishear: seventy and seventeen sound alike, and to the model seventeen is the
// likelier set. Whoever uses it reads back what was heard.
package voice
