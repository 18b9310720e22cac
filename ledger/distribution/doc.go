// Package distribution has the few probability distributions that the drying
// curve and the surveys need: normal, Student's t, beta, binomial and
// hypergeometric, their distribution functions and quantiles.
//
// Mathematics only, no words: methods are the textbook ones (continued
// fraction of the incomplete beta function, sums of logarithms of binomial
// coefficients), tests hold them to published tables. Out of its domain a
// function gives NaN.
//
// The package imports nothing of ours.
package distribution
