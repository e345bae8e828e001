package bot

import (
	"bytes"

	"dogleg/bot/cutlist"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// export hands over the list as a table, and as a sheet of paper for the truck.
func (t *turn) export(s parser.Statement) part {
	pieces := t.pieces()
	if len(pieces) == 0 {
		return t.tell(s, true, wording.ListEmpty)
	}
	with, _ := readStock("") // nothing to misread
	buys, err := t.buys(cutlist.Open(pieces), with)
	if err != nil {
		return t.refuse(s, errFault)
	}
	o := t.options(t.talk.Language)
	sheet := sketch.Truck(pieces, buys, t.message.When.Format("2 Jan 2006"), o)
	var paper bytes.Buffer
	if err := sheet.PDF(&paper, t.message.When); err != nil {
		t.conversation.log().Error("the sheet can't be made", "error", err)
		return t.refuse(s, errFault)
	}
	p := said(s, true, wording.Exported(pieces, o))
	p.files = []File{
		{Name: "cut-list" + t.stamp() + ".csv", Content: listTable(pieces, o)},
		{Name: "cut-list" + t.stamp() + ".pdf", Content: paper.Bytes()},
	}
	return p
}

func pngOf(s *sketch.Sheet) ([]byte, error) {
	var picture bytes.Buffer
	err := s.PNG(&picture)
	return picture.Bytes(), err
}
