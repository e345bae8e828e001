// Package walk lays the pieces of a line end to end in space and says where
// they land. It shares no formula with package geometry: it turns a heading
// about an axis and steps along it, as a person would walk the line.
package walk

import "dogleg/geometry"

// Point is a place in space: X along the old line, Y to the side, Z up.
type Point struct{ X, Y, Z geometry.Length }

// Path is a line walked piece by piece: the centers of its fittings and the
// ends of its pipes, in order.
type Path []Point
