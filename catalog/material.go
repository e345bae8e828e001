package catalog

// Material is what a pipe is made of. Its value is the word used in the JSON
// record of an answer.
type Material string

// The materials.
const (
	PVC      Material = "pvc"
	ABS      Material = "abs"
	CPVC     Material = "cpvc"
	Copper   Material = "copper"
	Steel    Material = "steel"
	CastIron Material = "cast-iron"
	PEX      Material = "pex"
	PP       Material = "pp"
	PE       Material = "pe"
)

// Joint is how two pieces are joined. It decides what takeoff means, how far
// the pipe goes in and which gap belongs.
type Joint string

// The joints.
const (
	Solvent    Joint = "solvent cement"
	Solder     Joint = "solder"
	Thread     Joint = "threaded"
	ButtWeld   Joint = "butt-weld"
	SocketWeld Joint = "socket-weld"
	NoHub      Joint = "no-hub"
	Hub        Joint = "hub-and-spigot"
	Crimp      Joint = "crimp"
	PushFit    Joint = "push-fit" // a ring seals the pipe in a socket
	Fusion     Joint = "fusion"   // plain ends, welded to each other or in a coupling
)

// Use is what a line carries, where the same material is sold in one pattern
// of fitting for drains and in another for pressure.
type Use string

// The uses.
const (
	DWV      Use = "DWV" // drain, waste and vent
	Pressure Use = "pressure"
	Sewer    Use = "sewer"
)

// Size is the trade's name of a pipe size: "1-1/2", "3/4", or of a metric one
// "110 mm". It is a name, never a measurement; nothing adds it. The empty Size
// is a size that nobody has said.
type Size string

// Pipe is a pipe as far as someone has said what it is; an empty field was not
// said. [Match] finds the systems that it can be.
type Pipe struct {
	Material Material
	Joint    Joint
	Use      Use
	Schedule string // "40", "80", "K", "L", "M", "SV", "XH", "SDR 35"
	Size     Size
}
