using System.Globalization;
using System.Text.RegularExpressions;

namespace TransportPlanner.Core.Tests.Reference;

/// <summary>
/// Recomputes a printed working from its own numbers: statements are parted by semicolons, words up to a colon are a label, units are
/// skipped, and what stands before each equals sign must give what stands after it. Whole minutes must be the result rounded down, or
/// up where the label says so.
/// </summary>
internal static partial class WorkingReader
{
    /// <param name="working">What is printed; ≈ counts as =.</param>
    /// <param name="isStrict">An equals sign means the very number that is printed, ≈ one that is not.</param>
    /// <returns>How many equations were recomputed.</returns>
    internal static int Recompute(string working, bool isStrict = false)
    {
        var count = 0;
        foreach (var statement in working.Split(';'))
        {
            var text = statement[(statement.LastIndexOf(':') + 1)..];
            if (text.Split('=', '≈') is not [var left, var right])
                continue;
            count++;
            var expected = Numeral().Match(right);
            Assert.True(expected.Success, statement);
            var (computed, printed) = (Evaluate(left), double.Parse(expected.Value, CultureInfo.InvariantCulture));
            if (isStrict)
                Assert.True(text.Contains('=') == Math.Abs(computed - printed) <= 1e-9 * Math.Abs(printed), $"{statement} gives {computed}");
            if (left.Contains('÷') && right.Trim().EndsWith(" min", StringComparison.Ordinal) && !left.Contains("ln"))
            {
                Assert.True(Math.Floor(computed + 1e-9 * computed) == printed || Math.Floor(computed) == printed, $"{statement} gives {computed}");
            }
            else
            {
                var decimals = expected.Value.Contains('.') ? expected.Value.Length - expected.Value.IndexOf('.') - 1 : 3;
                Assert.True(Math.Abs(computed - printed) <= Math.Pow(10, -Math.Min(decimals, 3)) + 2e-6 * Math.Abs(printed), $"{statement} gives {computed}");
            }
        }

        return count;
    }

    private static double Evaluate(string text)
    {
        var tokens = Token().Matches(text.Replace(",", "")).Select(match => match.Value).ToList();
        var at = 0;
        var value = Sum();
        Assert.Equal(tokens.Count, at);
        return value;

        double Sum()
        {
            var sum = Product();
            while (at < tokens.Count && tokens[at] is "+" or "−")
                sum = tokens[at++] == "+" ? sum + Product() : sum - Product();
            return sum;
        }

        double Product()
        {
            var product = Factor();
            while (at < tokens.Count && tokens[at] is "×" or "÷")
                product = tokens[at++] == "×" ? product * Factor() : product / Factor();
            return product;
        }

        double Factor()
        {
            switch (tokens[at++])
            {
                case "−":
                    return -Factor();
                case "ln":
                    return Math.Log(Factor());
                case "exp":
                    return Math.Exp(Factor());
                case "(":
                    var inner = Sum();
                    Assert.Equal(")", tokens[at++]);
                    return inner;
                case var number:
                    return double.Parse(number, CultureInfo.InvariantCulture);
            }
        }
    }

    // Units such as L/psi, L/min and per h are letters and slashes that no alternative takes.
    [GeneratedRegex(@"\d+(\.\d+)?|ln|exp|[()+−×÷]")]
    private static partial Regex Token();

    [GeneratedRegex(@"\d+(\.\d+)?")]
    private static partial Regex Numeral();
}
