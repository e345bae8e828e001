package store

// This file is the book that a crew shares: takeoffs that serve everyone in a
// chat. Who may write in it is for the conversation to say.

// CrewTakeoffs returns the takeoffs that the people of this person's chat
// share, by system, fitting, size and line.
func (p *Person) CrewTakeoffs() []Takeoff { return p.tx.takeoffs(p.tx.crew(p.key.Chat())) }

// SetCrewTakeoff keeps a takeoff for everyone in the chat. Its length must be
// more than zero.
func (p *Person) SetCrewTakeoff(t Takeoff) {
	t.Setter = p.key.user()
	if p.tx.measured(t) {
		chat := p.tx.make(p.tx.root.Bucket(crewsBucket), []byte(p.key.Chat()))
		p.tx.put(p.tx.make(chat, takeoffsBucket), t.key(), t)
		if t.Setter != "" {
			p.tx.enter(p.key)
		}
	}
}

// ForgetCrewTakeoff takes one away for everyone in the chat, found by its
// system, fitting, size and line. It is false if there was none.
func (p *Person) ForgetCrewTakeoff(t Takeoff) bool {
	return p.tx.remove(p.tx.crew(p.key.Chat()), t.key())
}

// crew is the book of a chat, nil if it has none.
func (tx *Tx) crew(chat Chat) *bucket {
	return tx.root.Bucket(crewsBucket).Bucket([]byte(chat)).Bucket(takeoffsBucket)
}

// moveCrew gives the book of a chat to its new name. A chat that already has
// one under that name keeps it.
func (tx *Tx) moveCrew(from, to Chat) {
	crews := tx.root.Bucket(crewsBucket)
	if tx.err != nil || crews.Bucket([]byte(from)) == nil {
		return
	}
	if crews.Bucket([]byte(to)) == nil {
		copyBucket(tx, crews.Bucket([]byte(from)), tx.make(crews, []byte(to)))
		tx.eachSetter(to, tx.enter)
	}
	tx.eachSetter(from, tx.leave)
	tx.fail(crews.DeleteBucket([]byte(from)))
}

// eachSetter does something with the key of each who set a takeoff in the book of
// a chat.
func (tx *Tx) eachSetter(chat Chat, do func(Key)) {
	for _, t := range tx.takeoffs(tx.crew(chat)) {
		if k, known := t.setter(chat); known {
			do(k)
		}
	}
}
