package voice

import (
	"bytes"
	"compress/gzip"
	_ "embed" // the model
	"io"
	"os"
	"path/filepath"
)

// The model is made by the command in the folder teach; see there.

//go:embed model/trade.lm.gz
var languageModel []byte

//go:embed model/trade.dict.gz
var dictionary []byte

const (
	modelFile      = "trade.lm"
	dictionaryFile = "trade.dict"
)

// unpackModel writes the files of the model where the recognizer can read them.
func unpackModel(folder string) error {
	for name, packed := range map[string][]byte{modelFile: languageModel, dictionaryFile: dictionary} {
		r, err := gzip.NewReader(bytes.NewReader(packed))
		if err != nil {
			return err
		}
		content, err := io.ReadAll(r)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(folder, name), content, 0o600); err != nil {
			return err
		}
	}
	return nil
}
