package cutlist

import (
	"errors"
	"time"

	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/store"
)

// Recipe is what a picture of the list, or a sheet of paper, is made of. It is
// kept until the file is sent, maybe by another version of this program.
type Recipe struct {
	Of     Dish            `json:"-"`
	Pieces []store.Cut     `json:",omitempty"`
	Stock  geometry.Length `json:",omitempty"`
	Saw    Saw             `json:",omitzero"`
	Pipe   catalog.Pipe    `json:",omitzero"`
	Code   string          `json:",omitempty"` // that hangers go by
}

// Dish is what a recipe is of.
type Dish string

// The dishes.
const (
	TheSticks   Dish = "sticks"
	TheTruck    Dish = "truck"
	TheMaterial Dish = "material"
)

// errNoDish says that a recipe is of nothing that the list can show.
var errNoDish = errors.New("cutlist: a recipe of nothing")

// Sheet is what a recipe makes, on a day.
func (r Recipe) Sheet(when time.Time, o wording.Options) (*sketch.Sheet, error) {
	pieces := piecesOf(r.Pieces)
	with := stock{length: r.Stock, saw: r.Saw, named: true, pipe: r.Pipe}
	if r.Of == TheMaterial {
		needs, err := materialsOf(Open(pieces), with, r.Code)
		return MaterialSheet(needs, o), err
	}
	buys, err := buysOf(Open(pieces), with)
	switch {
	case err != nil:
		return nil, err
	case r.Of == TheSticks:
		return PlanSheet(buys, r.Saw, o), nil
	case r.Of == TheTruck:
		return TruckSheet(pieces, buys, when.Format("2 Jan 2006"), o), nil
	}
	return nil, errNoDish
}
