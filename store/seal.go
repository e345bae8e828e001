package store

import (
	"encoding/binary"
	"hash/crc32"
)

// A value in the file is followed by a checksum of it and its key, so that rot is seen:
// a flipped bit may leave JSON that reads well, with another length in it. Values of
// earlier versions have none until they are written again. One whose checksum is wrong
// is read as it stands, with the checksum behind it: as JSON that can't be read, it is
// the mishap of those alone whom it concerns, and Check names it.

// sealMark stands before a checksum. No JSON has it, nor has any other value of ours.
const sealMark = 0x1E

const (
	sealLong = 5 // mark and checksum, in bytes
	unsealed = 8 // values of so many bytes are numbers, and have none
)

// sealsFrom is the version of the schema that has checksums.
const sealsFrom = 5

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func sealOf(key, value []byte) uint32 {
	return crc32.Update(crc32.Checksum(key, castagnoli), castagnoli, value)
}

// sealed is a value as it stands in the file.
func sealed(key, value []byte) []byte {
	if len(value) <= unsealed {
		return value
	}
	with := make([]byte, 0, len(value)+sealLong)
	with = append(append(with, value...), sealMark)
	return binary.LittleEndian.AppendUint32(with, sealOf(key, value))
}

// plain is a value without its checksum, where that is right.
func plain(key, stands []byte) []byte {
	if !looksSealed(stands) {
		return stands
	}
	value := stands[:len(stands)-sealLong]
	if binary.LittleEndian.Uint32(stands[len(value)+1:]) != sealOf(key, value) {
		return stands
	}
	return value
}

func looksSealed(stands []byte) bool {
	return len(stands) > unsealed+sealLong && stands[len(stands)-sealLong] == sealMark
}

// seals notes those values in a bucket, and in all that are in it, whose checksum is
// wrong.
func (c *check) seals(where string, b *bucket) {
	if b == nil {
		return
	}
	cursor := b.bolt.Cursor()
	for k, stands := cursor.First(); k != nil; k, stands = cursor.Next() {
		switch {
		case stands == nil:
			c.seals(where+"/"+string(k), b.Bucket(k))
		case looksSealed(stands) && len(plain(k, stands)) == len(stands):
			c.wrong("%s: %q has a wrong checksum", where, k)
		}
	}
}
