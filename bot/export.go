package bot

import (
	"dogleg/bot/cutlist"
	"dogleg/parser"
)

// export hands over the list as a table, and as a sheet of paper for the truck.
func (t *turn) export(s parser.Statement) part {
	cuts := t.listMemory().Cuts()
	pieces := piecesOf(cuts)
	if len(pieces) == 0 {
		return said(s, true, t.sayOfList("list empty"))
	}
	with, _ := readStock("") // nothing to misread
	if _, err := buysOf(cutlist.Open(pieces), with); err != nil {
		return t.refuse(s, errFault)
	}
	o := t.options(t.talk.Language)
	p := said(s, true, cutlist.Exported(pieces, o))
	p.files = []File{{Name: "cut-list" + t.stamp() + ".csv", Content: listTable(pieces, o)}}
	r := recipe{Of: theTruck, Options: o, Pieces: cuts, Saw: with.saw, When: t.message.When}
	p.files = append(p.files, t.toBePainted(r, "cut-list"+t.stamp()+".pdf", false)...)
	return p
}
