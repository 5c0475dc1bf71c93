import { expect, test } from "vitest";
import {
  chiSquaredBelow,
  chiSquaredQuantile,
  normalBelow,
  normalQuantile,
  tBelow,
  tQuantile,
} from "../../src/chance/index.ts";

// Reference values: roots of the incomplete beta and gamma functions at 30 digits (mpmath 1.3.0, computed).
test.each([
  [0.975, 1, 12.7062047361747],
  [0.975, 4, 2.77644510519779],
  [0.975, 10, 2.22813885198627],
  [0.995, 16, 2.9207816224251],
  [0.9, 2.5, 1.73025092880718],
  [0.999, 30, 3.38518486682931],
])("t quantile at %f with %f degrees of freedom is %f", (p, dof, quantile) => {
  // 1e-12: a hundred times the last digit written.
  expect(tQuantile(p, dof) / quantile).toBeCloseTo(1, 12);
  expect(tBelow(quantile, dof)).toBeCloseTo(p, 12);
});

test.each([
  [0.95, 3, 7.81472790325118],
  [0.999, 25, 52.6196557761728],
])("chi-squared quantile at %f with %f degrees of freedom is %f", (p, dof, quantile) => {
  expect(chiSquaredQuantile(p, dof) / quantile).toBeCloseTo(1, 12);
  expect(chiSquaredBelow(quantile, dof)).toBeCloseTo(p, 12);
});

test("the t distribution of endless degrees of freedom is the normal one", () => {
  expect(normalQuantile(0.975)).toBeCloseTo(1.95996398454005, 13);
  expect(tQuantile(0.975, Number.POSITIVE_INFINITY)).toBe(normalQuantile(0.975));
  expect(tBelow(1.3, Number.POSITIVE_INFINITY)).toBe(normalBelow(1.3));
});

test("shares outside 0 to 1 and degrees of freedom at or below zero are refused", () => {
  expect(() => normalQuantile(0)).toThrow("probability: 0; a number between 0 and 1 is expected");
  expect(() => tQuantile(0.5, 0)).toThrow("degrees of freedom: 0; a number above zero is expected");
});
