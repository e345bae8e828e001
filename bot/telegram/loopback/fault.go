package loopback

import (
	"fmt"
	"net/http"
	"strconv"
	"time"
)

// Fault is something that goes wrong with a call, once unless Times says
// otherwise. Faults are used up in the order planted.
type Fault struct {
	Method string // that it strikes; "" any
	Chat   int64  // that it strikes; 0 any
	Times  int    // 0 is once; negative is for ever

	Delay time.Duration // wait so long first
	Hang  bool          // then say nothing until the caller gives up
	Half  bool          // let it take effect, then break off in mid-response; with Hang, stop there until the caller gives up
	Lost  bool          // let it take effect, then break off before a response

	Status  int    // respond with this status
	Body    string // and these bytes, and don't let it take effect
	Waiting int    // seconds for the Retry-After header
}

// Plant makes a fault strike from now on.
func (s *Server) Plant(f Fault) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if f.Times == 0 {
		f.Times = 1
	}
	s.faults = append(s.faults, &f)
}

// TooMany is 429, to be tried again after so many seconds.
func TooMany(method string, seconds int) Fault {
	return Fault{
		Method: method, Status: http.StatusTooManyRequests, Waiting: seconds,
		Body: fmt.Sprintf(`{"ok":false,"error_code":429,"description":"Too Many Requests: retry after %d","parameters":{"retry_after":%d}}`, seconds, seconds),
	}
}

// BadGateway is the page that a proxy in front of the server shows.
func BadGateway(method string) Fault {
	return Fault{
		Method: method, Status: http.StatusBadGateway,
		Body: "<html>\r\n<head><title>502 Bad Gateway</title></head>\r\n<body><center><h1>502 Bad Gateway</h1></center></body>\r\n</html>",
	}
}

// Refuse is a refusal in the server's own form.
func Refuse(method string, code int, description string) Fault {
	return Fault{
		Method: method, Status: code,
		Body: fmt.Sprintf(`{"ok":false,"error_code":%d,"description":%q}`, code, description),
	}
}

func (s *Server) fault(c Call) *Fault {
	s.mu.Lock()
	defer s.mu.Unlock()
	chat, _ := strconv.ParseInt(c.Params["chat_id"], 10, 64)
	for _, f := range s.faults {
		if f.Times == 0 || (f.Method != "" && f.Method != c.Method) || (f.Chat != 0 && f.Chat != chat) {
			continue
		}
		f.Times--
		return f
	}
	return &Fault{}
}

// before does what goes wrong ahead of the call and says whether the call
// still takes place.
func (f *Fault) before(s *Server, w http.ResponseWriter, r *http.Request, c Call) bool {
	s.wait(r, f.Delay)
	if f.Hang && !f.Half {
		s.record(c, 0, "no response")
		s.wait(r, time.Hour)
		return false
	}
	if f.Status == 0 {
		return true
	}
	s.record(c, f.Status, "planted: "+f.Body)
	if f.Waiting > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(f.Waiting))
	}
	w.WriteHeader(f.Status)
	_, _ = w.Write([]byte(f.Body))
	return false
}

// after breaks off the response to a call that took effect, or says that it
// may go out whole.
func (f *Fault) after(s *Server, w http.ResponseWriter, r *http.Request, c Call) bool {
	if !f.Half && !f.Lost {
		return true
	}
	s.record(c, 0, "broken off")
	if f.Half {
		w.Header().Set("Content-Length", "4096")
		_, _ = w.Write([]byte(`{"ok":true,"result":{"message_id":`))
	}
	if f.Hang {
		_ = http.NewResponseController(w).Flush()
		s.wait(r, time.Hour)
	}
	panic(http.ErrAbortHandler) // net/http's own way to drop a connection
}

// wait lets time pass until the caller leaves or the server closes.
func (s *Server) wait(r *http.Request, d time.Duration) {
	if d == 0 {
		return
	}
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
	case <-r.Context().Done():
	case <-s.gone:
	}
}

// Mend takes away every fault that was planted.
func (s *Server) Mend() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.faults = nil
}
