package store

import (
	"encoding/binary"
)

// KeptExchanges is for how many of a person's messages it is remembered which
// message answered them; the oldest go first.
const KeptExchanges = 100

// Exchange is a message of a person's and the message that answered it, by
// their numbers in the chat. It holds no words.
type Exchange struct {
	Question int64
	Answer   int64    // 0 until it is sent
	Jobs     []uint64 // that came of it
	More     []int64  `json:",omitempty"` // messages that go with the answer: its other parts, and files
	About    []uint64 `json:",omitempty"` // jobs that it is about and that came of another
}

// The buckets of a person's exchanges: by question, and the question of each
// answer.
var (
	exchangesBucket = []byte("exchanges")
	answersBucket   = []byte("answers")
)

// SetExchange keeps an exchange in the place of what was kept for its question.
func (p *Person) SetExchange(e Exchange) {
	b := p.madePart(exchangesBucket)
	more := b.Get(messageKey(e.Question)) == nil
	p.tx.put(b, messageKey(e.Question), e)
	for _, answer := range e.answers() {
		if answers := p.madePart(answersBucket); answers != nil {
			p.tx.fail(answers.Put(messageKey(answer), messageKey(e.Question)))
		}
	}
	if more {
		p.trimExchanges(b)
	}
}

// answers are all messages that answer.
func (e Exchange) answers() []int64 {
	if e.Answer == 0 {
		return e.More
	}
	return append([]int64{e.Answer}, e.More...)
}

// Exchange finds an exchange by its question. It is false if none is kept.
func (p *Person) Exchange(question int64) (e Exchange, ok bool) {
	ok = p.tx.get(p.part(exchangesBucket), messageKey(question), &e)
	return e, ok
}

// ExchangeBy finds an exchange by any of the messages that answer.
func (p *Person) ExchangeBy(answer int64) (Exchange, bool) {
	b := p.part(answersBucket)
	if b == nil {
		return Exchange{}, false
	}
	question := b.Get(messageKey(answer))
	if len(question) != 8 {
		return Exchange{}, false
	}
	return p.Exchange(int64(binary.BigEndian.Uint64(question)))
}

// PeopleIn lists the keys of all who keep something in a chat.
func (tx *Tx) PeopleIn(chat Chat) []Key {
	var keys []Key
	prefix := string(chat) + "/"
	for k := range tx.root.Bucket(peopleBucket).from([]byte(prefix)) {
		if Key(k).Chat() != chat {
			break
		}
		keys = append(keys, Key(k))
	}
	return keys
}

// messageKey is the key of a message. Messages of a chat are numbered upwards, so
// the keys are in the order in which they came.
func messageKey(message int64) []byte {
	return binary.BigEndian.AppendUint64(nil, uint64(message))
}

// trimExchanges drops the oldest exchanges beyond KeptExchanges.
func (p *Person) trimExchanges(b *bucket) {
	if p.tx.err != nil {
		return
	}
	over := -KeptExchanges
	for range b.all() {
		over++
	}
	for ; over > 0; over-- {
		k, v := b.first()
		var e Exchange
		if p.tx.decode(v, &e) {
			for _, answer := range e.answers() {
				p.tx.remove(p.part(answersBucket), messageKey(answer))
			}
		}
		p.tx.remove(b, k)
	}
}

// dropExchanges forgets the numbers of messages, which mean nothing in another
// chat.
func (p *Person) dropExchanges() {
	b := p.bucket()
	for _, name := range [][]byte{exchangesBucket, answersBucket} {
		if p.tx.err == nil && b != nil && b.Bucket(name) != nil {
			p.tx.fail(b.DeleteBucket(name))
		}
	}
}
