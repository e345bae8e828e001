package bot

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"dogleg/bot/cutlist"
	"dogleg/bot/figure"
	"dogleg/bot/sketch"
	"dogleg/bot/training"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/parser"
)

// A picture takes as long to be painted as a hundred answers, and a megabyte. So an
// answer only says what is to be on it, and it is painted when it is sent: nobody
// else's answer waits for that, and what waits to be sent is small.

// recipe is what a picture or a sheet is made of. It is kept until the file is sent,
// maybe by another version of this program.
type recipe struct {
	Of      dish
	Options wording.Options

	Ask      *parser.Ask      `json:",omitempty"` // of an answer
	Settings *figure.Settings `json:",omitempty"`

	listRecipe           // of the cut list
	When       time.Time `json:",omitzero"`

	System  string       `json:",omitempty"` // of a fitting to be measured: its catalog.System.ID
	Fitting string       `json:",omitempty"` // and its catalog.Fitting.Key
	Size    catalog.Size `json:",omitempty"`

	trainingRecipe // of a picture of the training
}

// The recipes of the rooms that have pictures of their own.
type (
	listRecipe     = cutlist.Recipe
	trainingRecipe = training.Recipe
)

// dish is what a recipe is of.
type dish string

const (
	anAnswer  dish = "answer"
	aTemplate dish = "template"
	theSticks dish = dish(cutlist.TheSticks)
	theTruck  dish = dish(cutlist.TheTruck)
	material  dish = dish(cutlist.TheMaterial)
	toMeasure dish = "measure"
)

// toBePainted is a file that is made when it is wanted.
func (t *turn) toBePainted(r recipe, name string, picture bool) []File {
	text, err := json.Marshal(r)
	if err != nil {
		t.conversation.log().Error("a picture can't be noted", "picture", name, "error", err)
		return nil
	}
	return []File{{Name: name, Picture: picture, Recipe: text}}
}

// Paint makes a file that has a recipe; any other is as it was. It is false where
// the file can't be made: a fault there costs the file only. What is too large for a
// picture becomes a sheet of paper.
func (c *Conversation) Paint(f File) (painted File, ok bool) {
	if f.Recipe == nil {
		return f, true
	}
	defer func() {
		if fault := recover(); fault != nil {
			c.report(fault)
			painted, ok = File{}, false
		}
	}()
	var r recipe
	err := json.Unmarshal(f.Recipe, &r)
	if err == nil {
		f.Content, err = wall.hang(r)
	}
	if errors.Is(err, sketch.ErrTooLarge) {
		f.Name, f.Picture = strings.TrimSuffix(f.Name, ".png")+".pdf", false
		f.Content, err = r.onPaper()
	}
	if err != nil {
		c.log().Error("a picture can't be made", "picture", f.Name, "error", err)
		return File{}, false
	}
	f.Recipe = nil
	return f, true
}

// make makes the file.
func (r recipe) make() ([]byte, error) {
	switch r.Of {
	case anAnswer:
		if r.Ask == nil || r.Settings == nil {
			return nil, errIncomplete
		}
		answer, err := figure.Solve(*r.Ask, *r.Settings)
		if err != nil {
			return nil, err
		}
		return pngOf(sketch.Draw(answer, r.Options))
	case theSticks, material:
		return pngOf(r.ofList())
	case theTruck, aTemplate:
		return r.onPaper()
	case toMeasure:
		return pngOf(r.measured())
	}
	return r.trainingRecipe.Make(training.Dish(r.Of), r.Options)
}

// errIncomplete says that a recipe lacks what its kind needs, or is of none.
var errIncomplete = errors.New("bot: an incomplete recipe")

// paper is what is written on sheets of paper.
type paper interface {
	PDF(w io.Writer, when time.Time) error
}

// onPaper makes a sheet of paper of the cut list, or of its sticks, or one to be
// wrapped around a pipe.
func (r recipe) onPaper() ([]byte, error) {
	var sheet paper
	err := sketch.ErrTooLarge // of pictures, whatever their size
	switch r.Of {
	case anAnswer:
	case aTemplate:
		sheet, err = r.template()
	case theSticks, theTruck, material:
		sheet, err = r.ofList()
	case toMeasure: // whatever its size, it is a picture
	}
	if sheet == nil && err == nil {
		err = errIncomplete
	}
	var printed bytes.Buffer
	if err == nil {
		err = sheet.PDF(&printed, r.When)
	}
	return printed.Bytes(), err
}

// template is the strip of an answer that is printed and wrapped around a pipe.
func (r recipe) template() (paper, error) {
	if r.Ask == nil || r.Settings == nil {
		return nil, errIncomplete
	}
	answer, err := figure.Solve(*r.Ask, *r.Settings)
	if err != nil {
		return nil, err
	}
	return sketch.TemplateOf(answer, r.Options)
}

// measured is the picture of a fitting that is to be measured.
func (r recipe) measured() (*sketch.Drawing, error) {
	system, known := catalog.SystemByID(r.System)
	f, ok := catalog.FittingByKey(r.Fitting)
	if !known || !ok {
		return nil, errIncomplete
	}
	return sketch.Measure(system, f, r.Size, r.Options)
}

// ofList is the picture or the sheet of paper that the cut list makes.
func (r recipe) ofList() (*sketch.Sheet, error) {
	r.listRecipe.Of = cutlist.Dish(r.Of)
	return r.Sheet(r.When, r.Options)
}

// pngOf is a picture of what could be drawn.
func pngOf[D interface{ PNG(io.Writer) error }](drawing D, err error) ([]byte, error) {
	var picture bytes.Buffer
	if err == nil {
		err = drawing.PNG(&picture)
	}
	return picture.Bytes(), err
}

// gallery keeps what was painted of words and bends: there are some dozens, and
// they are asked for again and again.
type gallery struct {
	mu       sync.Mutex
	pictures map[string][]byte
}

// wall is the gallery of this process: what is on its pictures is nobody's.
var wall gallery

// mostHung is how many pictures are kept, a few megabytes of them.
const mostHung = 200

// hang is a picture that hangs there already, or is painted now.
func (g *gallery) hang(r recipe) ([]byte, error) {
	if !r.trainingRecipe.Common(training.Dish(r.Of)) {
		return r.make()
	}
	of := fmt.Sprint(r.Of, r.Title, r.Options)
	g.mu.Lock()
	content := g.pictures[of]
	g.mu.Unlock()
	if content != nil {
		return content, nil
	}
	content, err := r.make()
	if err != nil {
		return nil, err
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	if len(g.pictures) < mostHung {
		if g.pictures == nil {
			g.pictures = map[string][]byte{}
		}
		g.pictures[of] = content
	}
	return content, nil
}
