package ask

import (
	"slices"

	"dogleg/catalog"
	"dogleg/geometry"
)

// GiveEnds gives the ends what was measured of fittings: one figure is of both ends,
// two are one each. A spigot is of a street fitting, an inlet and an outlet are of a
// branch fitting, where one is named.
func (a *Ask) GiveEnds() {
	for i := range a.Ends {
		e := &a.Ends[i]
		for role, to := range map[Role]*geometry.Length{
			TakeoffOf: &e.Takeoff, Face: &e.Face, Depth: &e.Depth, Spigot: &e.Spigot, Inlet: &e.Inlet, Outlet: &e.Outlet,
		} {
			if all := a.All(role); len(all) > 0 && (hasSide(e.Fitting, role) || !hasSide(a.Ends[1-i].Fitting, role)) {
				*to = all[min(i, len(all)-1)].Length
			}
		}
	}
}

// branches are the fittings with an inlet and an outlet that aren't alike.
var branches = []catalog.Shape{catalog.Wye, catalog.Combination, catalog.Tee, catalog.SanitaryTee, catalog.CleanoutTee}

// hasSide says whether a fitting has the side that a role is of.
func hasSide(f catalog.Fitting, r Role) bool {
	switch r {
	case Spigot:
		return f.Street
	case Inlet, Outlet:
		return slices.Contains(branches, f.Shape)
	}
	return true
}
