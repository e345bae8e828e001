// Package hearing picks what was said from the guesses of an ear, by what makes
// sense as a request, and says how sure that is.
//
// An ear knows how words sound; it does not know that a set of 14 is as good as
// one of 40, nor that "five" is a word and 5/8 PVC is no pipe. Here each guess
// is read as a message would be, guesses that mean the same are taken together,
// and those that mean nothing count as talk. [Judge.Choose] then says which meaning
// is likeliest and whether it may be answered at once.
//
// The probability of a meaning is that of each guess, times how surely the guess is
// read, summed over the guesses of all decoders. Number words that can be taken two
// ways are written in each. A meaning is sure above a probability that was chosen on
// recordings, if its wording leaves no word of the guess out and no number over.
// A teen that may have been a ty (seventeen, seventy) is never sure, nor is what
// would change what is kept of the person. All else is asked back, with up to
// three whole readings, those that can be figured first.
//
// What was heard is given in tape figures, "12-5/8 set 45s 1-1/2 pvc", so that
// it can be read at a glance, and sent back as it stands.
//
// # Caveats
//
// A wrong guess can be a good request; then nothing here notices. Whoever
// answers a note says first what was heard.
package hearing
