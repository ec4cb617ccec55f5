// Package manifest decodes the manifest that netrate cluster kubernetes writes, strictly, into the types of
// Kubernetes. It is a module of its own, so that netrate depends on none of them.
package manifest

import (
	"bytes"
	"os"
	"testing"

	batch "k8s.io/api/batch/v1"
	core "k8s.io/api/core/v1"
	"sigs.k8s.io/yaml"
)

const tasks = 50

func TestManifestIsOfKubernetes(t *testing.T) {
	text, err := os.ReadFile("../../cmd/netrate/testdata/clusters/kubernetes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	parts := bytes.Split(text, []byte("---\n")) // which no scenario of the test has
	if len(parts) != 3 {
		t.Fatalf("%d documents, want 3", len(parts))
	}
	var files core.ConfigMap
	var shards, merge batch.Job
	for i, to := range []any{&files, &shards, &merge} {
		if err := yaml.UnmarshalStrict(parts[i], to); err != nil {
			t.Fatalf("document %d: %v", i+1, err)
		}
	}
	line, err := os.ReadFile("../../cmd/netrate/testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if got := files.Data["line.yaml"]; got != string(line) {
		t.Errorf("the scenario is carried as\n%s", got)
	}
	s := shards.Spec
	if s.CompletionMode == nil || *s.CompletionMode != batch.IndexedCompletion || *s.Completions != tasks || s.BackoffLimitPerIndex == nil {
		t.Errorf("want %d indexed completions, each with attempts of its own: %+v", tasks, s)
	}
	rule := s.PodFailurePolicy.Rules[0]
	if rule.Action != batch.PodFailurePolicyActionFailJob || rule.OnExitCodes.Operator != batch.PodFailurePolicyOnExitCodesOpIn || rule.OnExitCodes.Values[0] != 2 {
		t.Errorf("want status 2 to fail the job at once: %+v", rule)
	}
	if s.Template.Spec.RestartPolicy != core.RestartPolicyNever {
		t.Error("a policy of failures wants pods that are never restarted")
	}
	if merge.Spec.Suspend == nil || !*merge.Spec.Suspend {
		t.Error("the merge must wait for the shards")
	}
	if err := yaml.UnmarshalStrict(bytes.Replace(parts[1], []byte("completions:"), []byte("completion:"), 1), &shards); err == nil {
		t.Error("a key that there is not goes unseen: this test cannot fail")
	}
}
