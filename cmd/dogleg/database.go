package main

import "dogleg/bot/serve"

// databaseFlag is the flag of those commands that work on a database which is
// there without being named.
type databaseFlag struct {
	DB string `name:"db" placeholder:"FILE" help:"Database file; else what DOGLEG_STORE or DOGLEG_DB names; else dogleg.db in your data folder."`
}

// in is the database that the flag and the environment name.
func (f databaseFlag) in(env func(string) string) serve.Database {
	return serve.Database{File: f.DB, Env: env}
}
