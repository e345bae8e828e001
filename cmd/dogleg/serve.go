package main

import (
	"context"

	"dogleg/bot/serve"
)

// serveCommand has no flag for the token on purpose: everyone on the machine
// sees a program's flags.
type serveCommand struct {
	databaseFlag
	CheckConfig bool `help:"Say of each setting whether it will do, and what would, and serve nothing."`
}

// Run serves until the context ends.
func (c serveCommand) Run(ctx context.Context, world streams) error {
	if c.CheckConfig {
		return serve.CheckConfig(c.in(world.env), world.out)
	}
	return serve.Run(ctx, c.in(world.env), world.err)
}
