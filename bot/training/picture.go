package training

import (
	"bytes"
	"errors"
	"io"

	"dogleg/bot/figure"
	"dogleg/bot/practice"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/geometry"
)

// What stands beside a text are pictures of what it says already: for a screen that
// can show them, and not worth a file otherwise.

// Dish is what a picture is of.
type Dish string

// The dishes.
const (
	ATriangle Dish = "triangle"
	AWord     Dish = "word"
	AnExam    Dish = "exam"
	AScore    Dish = "score"
	AProblem  Dish = "problem"
	AClass    Dish = "class" // a sheet of problems
)

// Picture is a picture or a sheet of paper that is made when it is sent.
type Picture struct {
	Of      Dish
	Name    string // of the file
	Options wording.Options
	Recipe
}

// Recipe is what a picture is made of, as far as its dish needs. It is kept until the
// file is sent, maybe by another version of this program.
type Recipe struct {
	Angle geometry.Angle     `json:",omitempty"`
	Title string             `json:",omitempty"`
	Exam  *practice.Exam     `json:",omitempty"`
	Score *practice.Training `json:",omitempty"`

	Problem *practice.Problem `json:",omitempty"`
	Class   *Class            `json:",omitempty"`
}

// ErrIncomplete says that a recipe lacks what its dish needs, or is of none.
var ErrIncomplete = errors.New("training: an incomplete recipe")

// Make makes a picture as a PNG image, and a sheet as a PDF.
func (r Recipe) Make(of Dish, o wording.Options) ([]byte, error) {
	switch of {
	case ATriangle:
		return pngOf(sketch.Triangle(r.Angle, r.Title, o))
	case AWord:
		return pngOf(sketch.Word(r.Title, Name(r.Title, o), o))
	case AnExam:
		if r.Exam != nil {
			return pngOf(examChart(r.Exam, o), nil)
		}
	case AScore:
		if r.Score != nil {
			return pngOf(scoreChart(*r.Score, o), nil)
		}
	case AProblem:
		if r.Problem != nil {
			return problemPNG(*r.Problem, o)
		}
	case AClass:
		if r.Class != nil {
			return r.Class.pdf(o)
		}
	}
	return nil, ErrIncomplete
}

func problemPNG(p practice.Problem, o wording.Options) ([]byte, error) {
	answer, err := figure.Solve(p.Ask(), figure.Settings{})
	if err != nil {
		return nil, err
	}
	return pngOf(unsolved(p, answer, o))
}

// Common says whether a picture shows the same to everybody.
func (r Recipe) Common(of Dish) bool { return of == ATriangle || of == AWord }

// pngOf is a picture of what could be drawn.
func pngOf[D interface{ PNG(io.Writer) error }](drawing D, err error) ([]byte, error) {
	var picture bytes.Buffer
	if err == nil {
		err = drawing.PNG(&picture)
	}
	return picture.Bytes(), err
}

func (r *Room) triangleOf(factor float64) []Picture {
	angle, title, ok := wording.Whence(factor, r.options())
	if !ok {
		return nil
	}
	return r.triangle(angle, title)
}

func (r *Room) triangleOfBend(angle geometry.Angle) []Picture {
	return r.triangle(angle, wording.BendName(angle))
}

func (r *Room) triangle(angle geometry.Angle, title string) []Picture {
	if _, err := sketch.Triangle(angle, title, r.options()); err != nil {
		return nil
	}
	return []Picture{{ATriangle, "triangle.png", r.options(), Recipe{Angle: angle, Title: title}}}
}

func (r *Room) pictureOf(question string) []Picture {
	word, ok := Word(question)
	if !ok {
		return nil
	}
	o := r.options()
	if _, err := sketch.Word(word, Name(word, o), o); err != nil {
		return nil
	}
	return []Picture{{AWord, "word.png", o, Recipe{Title: word}}}
}

func (r *Room) examChart(e *practice.Exam) []Picture {
	return []Picture{{AnExam, "exam.png", r.options(), Recipe{Exam: e}}}
}

func (r *Room) scoreChart() []Picture {
	t := r.State.Training
	if len(t.Tallies()) == 0 {
		return nil
	}
	score := practice.Training{Cards: t.Cards, Number: t.Number, Last: t.Last, Focus: t.Focus}
	return []Picture{{AScore, "score.png", r.options(), Recipe{Score: &score}}}
}
