package parser

// sense is a sort of meaning: that a word is a role's, a material's, that it links
// others. A word may have several.
type sense uint8

const (
	senseAnd sense = iota
	senseAngle
	senseArticle
	senseAsk
	senseAt
	senseBend
	senseBoth
	senseBy
	senseComeback
	senseCorrection
	senseCrew
	senseElsewhere
	senseFiller
	senseFitting
	senseFor
	senseFraction
	senseFromA
	senseFromWall
	senseHalfOf
	senseHandbook
	senseHint
	senseInto
	senseJoint
	senseLean
	senseLink
	senseMaterial
	senseMethod
	senseMine
	senseNext
	senseNot
	senseNumber
	senseObstacle
	senseOneEnd
	senseOperator
	senseOr
	senseOtherEnd
	sensePair
	sensePerFoot
	sensePerMeter
	sensePipe
	sensePlural
	senseRegular
	senseRole
	senseSchedule
	senseScheduled
	senseScrap
	senseSensitivity
	senseShortOf
	senseSide
	senseSize
	senseStreet
	senseStub
	senseSubtract
	senseSum
	senseSweep
	senseThen
	senseTo
	senseTouching
	senseUnit
	senseUse
	senseVerb
	senseWant
	senseWith
	senseOfReader // of the reader that comes
)

// senses are the names that the vocabulary has for them.
var senses = map[string]sense{
	"and":         senseAnd,
	"angle":       senseAngle,
	"article":     senseArticle,
	"ask":         senseAsk,
	"at":          senseAt,
	"bend":        senseBend,
	"both":        senseBoth,
	"by":          senseBy,
	"comeback":    senseComeback,
	"correction":  senseCorrection,
	"crew":        senseCrew,
	"elsewhere":   senseElsewhere,
	"filler":      senseFiller,
	"fitting":     senseFitting,
	"for":         senseFor,
	"fraction":    senseFraction,
	"from-a":      senseFromA,
	"from-wall":   senseFromWall,
	"half-of":     senseHalfOf,
	"handbook":    senseHandbook,
	"hint":        senseHint,
	"into":        senseInto,
	"joint":       senseJoint,
	"lean":        senseLean,
	"link":        senseLink,
	"material":    senseMaterial,
	"method":      senseMethod,
	"mine":        senseMine,
	"next":        senseNext,
	"not":         senseNot,
	"number":      senseNumber,
	"obstacle":    senseObstacle,
	"one-end":     senseOneEnd,
	"operator":    senseOperator,
	"or":          senseOr,
	"other-end":   senseOtherEnd,
	"pair":        sensePair,
	"per-foot":    sensePerFoot,
	"per-meter":   sensePerMeter,
	"pipe":        sensePipe,
	"plural":      sensePlural,
	"regular":     senseRegular,
	"role":        senseRole,
	"schedule":    senseSchedule,
	"scheduled":   senseScheduled,
	"scrap":       senseScrap,
	"sensitivity": senseSensitivity,
	"short-of":    senseShortOf,
	"side":        senseSide,
	"size":        senseSize,
	"street":      senseStreet,
	"stub":        senseStub,
	"subtract":    senseSubtract,
	"sum":         senseSum,
	"sweep":       senseSweep,
	"then":        senseThen,
	"to":          senseTo,
	"touching":    senseTouching,
	"unit":        senseUnit,
	"use":         senseUse,
	"verb":        senseVerb,
	"want":        senseWant,
	"with":        senseWith,
	"soft-number": senseOfReader,
	"point":       senseOfReader,
	"nominal":     senseOfReader,
}

// senseSet is a set of them: what a term may mean is asked for many times in every
// reading of it.
type senseSet uint64

func (s *senseSet) add(other sense)   { *s |= 1 << other }
func (s senseSet) has(one sense) bool { return s>>one&1 != 0 }
