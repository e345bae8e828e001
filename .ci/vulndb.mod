// The database of known vulnerabilities, which is served as a module. .ci/run
// reads it from the module cache; nothing is built from it.
module dogleg/ci

go 1.26.0

require golang.org/x/vulndb v0.0.0-20261105234957-e22db6528018
