//go:build !js

package main

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"html/template"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"

	_ "embed"

	"github.com/holdingfix/abeam/examples/internal/program"
	"github.com/holdingfix/abeam/examples/internal/whole"
)

//go:embed page.html
var pageText string

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	p := program.New("page", "builds a web page that computes holds in the browser.", stdout, stderr)
	out := p.Flags.String("out", "hold.html", "the `file` to write the page to")
	if code, ok := p.Parse(args); !ok {
		return code
	}
	page, err := build()
	if err == nil {
		err = whole.Write(*out, page)
	}
	if err != nil {
		return p.Fail(program.Failed, err)
	}
	return p.Print(fmt.Appendf(nil, "%s\n%s, %.1f MB\n", program.Caution, *out, float64(len(page))/1e6))
}

// build gives the page with the module and the support that Go's distribution has for it.
func build() ([]byte, error) {
	folder, err := os.MkdirTemp("", "page")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	file := filepath.Join(folder, "hold.wasm")
	if err := compile(file); err != nil {
		return nil, err
	}
	module, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	support, err := supportFile()
	if err != nil {
		return nil, err
	}
	script, err := os.ReadFile(support)
	if err != nil {
		return nil, err
	}
	page, err := template.New("page").Parse(pageText)
	if err != nil {
		return nil, err
	}
	var text bytes.Buffer
	err = page.Execute(&text, struct {
		Caution         string
		Support, Module template.JS // both were just made by the Go that runs here
	}{program.Caution, template.JS(script), template.JS(strconv.Quote(base64.StdEncoding.EncodeToString(module)))})
	return text.Bytes(), err
}

// compile builds the module of this program.
func compile(file string) error {
	cmd := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w", "-o", file, "github.com/holdingfix/abeam/examples/page")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	_, err := output(cmd)
	return err
}

// supportFile names the script that starts modules of the Go that is installed.
func supportFile() (string, error) {
	root, err := output(exec.Command("go", "env", "GOROOT"))
	return filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"), err
}

func output(cmd *exec.Cmd) (string, error) {
	out, err := cmd.Output()
	if failed, ok := errors.AsType[*exec.ExitError](err); ok {
		err = fmt.Errorf("%v: %w: %s", cmd, err, bytes.TrimSpace(failed.Stderr))
	}
	return string(out), err
}
