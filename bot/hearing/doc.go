// Package hearing picks what was said from the guesses of an ear, by what makes
// sense as a request, and says how sure that is.
//
// An ear knows how words sound; it does not know that a set of 14 is as good as
// one of 40, nor that "five" is a word and 5/8 PVC is no pipe. Here each guess
// is read as a message would be, guesses that mean the same are taken together,
// and those that mean nothing are put behind. [Choose] then says which meaning
// is likeliest and whether it may be answered at once.
//
// It is sure only where every decoder's best guess means the same, none of them
// has a word that no request has, and no other meaning lies near. A teen that
// may have been a ty (seventeen, seventy) needs more distance than other words,
// and what would throw something away is never sure. All else is asked back,
// with the likely readings.
//
// What was heard is given in tape figures, "12-5/8 set 45s 1-1/2 pvc", so that
// it can be read at a glance, and sent back as it stands.
//
// # Caveats
//
// A wrong guess can be a good request; then nothing here notices. Whoever
// answers a note says first what was heard.
package hearing
