package main

import (
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A block is what a page has between two lines of ```.
type block struct {
	language, text string
	line           int
}

func blocksOf(page string) []block {
	var out []block
	inside := false
	for i, line := range strings.Split(page, "\n") {
		switch language, fence := strings.CutPrefix(line, "```"); {
		case fence && !inside:
			out, inside = append(out, block{language: language, line: i + 1}), true
		case fence:
			inside = false
		case inside:
			out[len(out)-1].text += line + "\n"
		}
	}
	return out
}

// TestDocuments runs every command and snippet of the documents exactly as it is
// printed, one after another in one folder:
//
//   - bash: each line is a command, for which the command built here is on the
//     path. A remark above it that ends in "exit code 2" says with which it ends;
//     without one it is 0.
//   - text: what the commands or the program above it print, or a part of that; a
//     line of three dots stands for lines that are left out. With -update the block
//     is written anew, from its first line to its last.
//   - yaml: a file that the commands below it read; its first line is a remark
//     with its name. Without a name it is a part of a rule file.
//   - go: a whole program.
func TestDocuments(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "js" {
		t.Skip("the commands are written for bash")
	}
	if testing.Short() {
		t.Skip("it builds the command and the programs of the documents")
	}
	root, err := filepath.Abs(filepath.Join("..", ".."))
	require.NoError(t, err)
	bin := t.TempDir()
	out, err := exec.Command("go", "build", "-o", bin, ".").CombinedOutput()
	require.NoError(t, err, "%s", out)
	for _, name := range []string{"README.md", "examples/README.md", "examples/wrenfold/README.md", "rules/README.md"} {
		t.Run(name, func(t *testing.T) {
			r := &reader{root: root, bin: bin, dir: t.TempDir(), page: filepath.Join(root, name)}
			page, err := os.ReadFile(r.page)
			require.NoError(t, err)
			for _, link := range []string{"examples", "rules"} {
				require.NoError(t, os.Symlink(filepath.Join(root, link), filepath.Join(r.dir, link)))
			}
			blocks := blocksOf(string(page))
			require.NotEmpty(t, blocks)
			for _, b := range blocks {
				r.block(t, b)
			}
		})
	}
}

// reader does what a page says.
type reader struct {
	root, bin, dir, page string
	printed              string // by what was run last
}

func (r *reader) block(t *testing.T, b block) {
	t.Helper()
	switch b.language {
	case "bash":
		r.commands(t, b)
	case "text":
		if *update {
			b.text = r.anew(t, b)
		}
		rest := r.printed
		for part := range strings.SplitSeq("\n"+b.text, "\n...\n") {
			part = strings.Trim(part, "\n")
			_, after, found := strings.Cut(rest, part)
			require.True(t, found, "line %d: this was not printed:\n%s\nbut:\n%s", b.line, part, rest)
			rest = after
		}
	case "yaml":
		r.file(t, b)
	case "go":
		r.program(t, b)
	default:
		t.Errorf("line %d: a block of %q, which nothing tries", b.line, b.language)
	}
}

// anew writes a text block anew: what was printed from its first line to its last.
func (r *reader) anew(t *testing.T, b block) string {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(b.text, "\n"), "\n")
	first, last := lines[0]+"\n", "\n"+lines[len(lines)-1]+"\n"
	from := strings.Index("\n"+r.printed, "\n"+first)
	if len(lines) < 2 || from < 0 || strings.Contains(b.text, "\n...\n") {
		return b.text
	}
	to := strings.Index(r.printed[from:], last)
	if to < 0 {
		return b.text
	}
	text := r.printed[from : from+to+len(last)]
	page, err := os.ReadFile(r.page)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(r.page, []byte(strings.Replace(string(page), "\n```text\n"+b.text+"```", "\n```text\n"+text+"```", 1)), 0o644))
	return text
}

var ends = regexp.MustCompile(`^#.*exit code ([0-9])\.?$`)

func (r *reader) commands(t *testing.T, b block) {
	t.Helper()
	want := 0
	r.printed = ""
	for i, line := range strings.Split(strings.TrimSpace(b.text), "\n") {
		if m := ends.FindStringSubmatch(line); m != nil {
			want, _ = strconv.Atoi(m[1])
		}
		if strings.HasPrefix(line, "#") || line == "go test ./..." { // which runs this test
			continue
		}
		cmd := exec.Command("bash", "-c", line)
		if cmd.Dir = r.dir; strings.HasPrefix(line, "go ") {
			cmd.Dir = r.root
		}
		cmd.Env = append(os.Environ(), "PATH="+r.bin+string(os.PathListSeparator)+os.Getenv("PATH"), "GOBIN="+r.bin)
		out, err := cmd.CombinedOutput()
		code := 0
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			code = exit.ExitCode()
		} else {
			require.NoError(t, err)
		}
		require.Equal(t, want, code, "line %d: %s\n%s", b.line+i+1, line, out)
		r.printed += string(out)
		want = 0
	}
}

func (r *reader) file(t *testing.T, b block) {
	t.Helper()
	if first, _, _ := strings.Cut(b.text, "\n"); strings.HasPrefix(first, "# ") {
		path := filepath.Join(r.dir, strings.TrimPrefix(first, "# "))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(b.text), 0o644))
		return
	}
	files, err := filepath.Glob(filepath.Join(r.root, "rules", "*.yaml"))
	require.NoError(t, err)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		if strings.Contains(string(data), b.text) {
			return
		}
	}
	t.Errorf("line %d: no rule file has this:\n%s", b.line, b.text)
}

// program runs a program in a folder that the module does not have.
func (r *reader) program(t *testing.T, b block) {
	t.Helper()
	dir := t.TempDir()
	source, overlay := filepath.Join(dir, "main.go"), filepath.Join(dir, "overlay.json")
	require.NoError(t, os.WriteFile(source, []byte(b.text), 0o644))
	data, err := json.Marshal(map[string]map[string]string{"Replace": {filepath.Join(r.root, "cmd", "snippet", "main.go"): source}})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(overlay, data, 0o644))
	cmd := exec.Command("go", "run", "-overlay="+overlay, "./cmd/snippet")
	cmd.Dir = r.root
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "line %d: %s", b.line, out)
	r.printed = string(out)
}

// The two commands that the README begins with are these, and a prompt cannot be
// pasted.
func TestREADMEBegins(t *testing.T) {
	page, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	first := blocksOf(string(page))[0]
	require.Equal(t, "bash", first.language)
	require.Equal(t, "go run ./cmd/groundrule design examples/jobs/patio-on-stiff-clay.yaml\ngo test ./...\n", first.text)
	require.NotContains(t, string(page), "\n$ ")
}
