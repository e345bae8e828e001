package cutlist

// export hands over the list as a table, and as a sheet of paper for the truck.
func (l *List) export() (Part, error) {
	cuts := l.Kept.Cuts()
	pieces := piecesOf(cuts)
	if len(pieces) == 0 {
		return l.tell(true, "list empty"), nil
	}
	with, _ := readStock("") // nothing to misread
	with = with.on(Open(pieces))
	if _, err := buysOf(Open(pieces), with); err != nil {
		return Part{}, err
	}
	o := l.Talk.Options()
	p := said(true, exportedWords(pieces, o))
	p.Files = []File{
		{Name: "cut-list" + l.stamp() + ".csv", Content: listTable(pieces, o)},
		{Name: "cut-list" + l.stamp() + ".pdf", Recipe: &Recipe{Of: TheTruck, Pieces: cuts, Saw: with.saw}},
	}
	return p, nil
}
