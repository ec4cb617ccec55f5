package desk

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/money"
	"netrate/model/worth"
	"netrate/scenarios"
)

// Why nothing is said of a year is the true reason: a file with volumes of its jobs has volumes.
func TestWithoutYearSaysTheReason(t *testing.T) {
	assert.Empty(t, WithoutYear(&scenarios.Scenario{}))
	assert.Contains(t, WithoutYear(&scenarios.Scenario{Shop: scenarios.Shop{Prices: &worth.Costs{}}}), "have no volume")
	of := &worth.Costs{Volumes: map[string]money.Value{"letters": money.Fixed(1e6)}}
	said := WithoutYear(&scenarios.Scenario{Shop: scenarios.Shop{Prices: of}})
	assert.NotContains(t, said, "no volume")
	assert.Contains(t, said, "have volumes of all its jobs: of one alone")
	assert.Empty(t, WithoutYear(&scenarios.Scenario{Shop: scenarios.Shop{Prices: of, Costs: of}}))
}
