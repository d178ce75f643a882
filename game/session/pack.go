package session

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"io"

	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// Pack writes a text small and in letters that an address may hold: deflated,
// then base64 with - and _.
func Pack(text []byte) string {
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.BestCompression)
	if err != nil {
		panic("session: " + err.Error())
	}
	_, _ = w.Write(text) // a buffer takes everything
	_ = w.Close()
	return base64.RawURLEncoding.EncodeToString(b.Bytes())
}

// Unpack reads what Pack wrote; of anything else, and of a text larger than
// any file, it says that the address is damaged.
func Unpack(packed string) ([]byte, error) {
	damaged := Refusal{phrase.Of("stage.bad-address")}
	raw, err := base64.RawURLEncoding.DecodeString(packed)
	if err != nil {
		return nil, damaged
	}
	text, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(raw)), document.MaxBytes+1))
	if err != nil || len(text) > document.MaxBytes {
		return nil, damaged
	}
	return text, nil
}
