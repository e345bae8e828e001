// Package training is what the conversation says to an apprentice: it poses the
// problems of package practice and says how replies were marked, holds the exam,
// tells the score, explains words of the trade and the rules behind a step.
//
//	bot ──▶ Room ──▶ practice   makes, marks, schedules
//	 ▲       │ ├───▶ wording    how lengths, asks and steps are said
//	 └─Reply─┘ └───▶ sketch     pictures, painted when they are sent
//
// A [Room] is one message on its way through the training. What it needs of the
// conversation around it is [Talk]; what comes of it is a [Reply]. It keeps nothing
// itself: [State] is kept with the person, [Group] with a chat of several people.
//
// The sentences (sentences.go) and the words of the trade (glossary.csv) are of this
// package alone, in English and Spanish.
package training
