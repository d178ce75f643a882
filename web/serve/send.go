package serve

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"time"
)

// send writes content, or 304 when the reader has it. The tag is of the bytes
// sent, so a compressed copy has its own, as the protocol wants.
func send(w http.ResponseWriter, r *http.Request, content []byte, modified time.Time) {
	sum := sha256.Sum256(content)
	w.Header().Set("ETag", `"`+hex.EncodeToString(sum[:12])+`"`)
	if w.Header().Get("Content-Encoding") != "" {
		// ServeContent leaves the length out when the content is encoded.
		w.Header().Set("Accept-Ranges", "none")
		r.Header.Del("Range")
	}
	http.ServeContent(w, r, "", modified, bytes.NewReader(content))
}
