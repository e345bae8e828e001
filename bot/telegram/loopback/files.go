package loopback

import (
	"net/http"
	"strings"
	"time"
)

// largestFile is what the server gives out at most.
const largestFile = 20 << 20

// folder is where the server says that files are.
const folder = "voice/"

// Keep makes a file that messages can have: its number goes into their fields.
func (s *Server) Keep(file string, content []byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.files[file] = content
}

func (s *Server) getFile(p map[string]string) outcome {
	content, known := s.files[p["file_id"]]
	switch {
	case !known:
		return refused(400, "Bad Request: wrong file_id or the file is temporarily unavailable")
	case len(content) > largestFile:
		return refused(400, "Bad Request: file is too big")
	}
	return outcome{result: map[string]any{
		"file_id": p["file_id"], "file_unique_id": "u" + p["file_id"],
		"file_size": len(content), "file_path": folder + p["file_id"],
	}}
}

// serveFile gives out a file, by an address that has the token in it. It is a
// call of the method "file" to faults, and no call to Calls.
func (s *Server) serveFile(w http.ResponseWriter, r *http.Request, path string) {
	fault := s.fault(Call{Method: "file"})
	s.wait(r, fault.Delay)
	if fault.Hang {
		s.wait(r, time.Hour)
		return
	}
	s.mu.Lock()
	content, known := s.files[strings.TrimPrefix(path, folder)]
	s.mu.Unlock()
	switch {
	case fault.Status != 0:
		http.Error(w, fault.Body, fault.Status)
	case fault.Lost:
		panic(http.ErrAbortHandler)
	case !known:
		http.NotFound(w, r)
	default:
		_, _ = w.Write(content)
	}
}
