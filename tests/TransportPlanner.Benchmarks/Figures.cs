using System.Diagnostics;
using System.Runtime.InteropServices;

namespace TransportPlanner.Benchmarks;

/// <summary>Measuring and printing, alike in every benchmark.</summary>
internal static class Figures
{
    /// <summary>The value at position floor(n · percent / 100) of the sorted values: at least that share of them is no larger.</summary>
    public static double Percentile(IEnumerable<double> values, int percent)
    {
        double[] sorted = [.. values.Order()];
        return sorted[Math.Min(sorted.Length - 1, sorted.Length * percent / 100)];
    }

    public static double Milliseconds(Action action)
    {
        var start = Stopwatch.GetTimestamp();
        action();
        return Since(start);
    }

    public static double Since(long start) => Stopwatch.GetElapsedTime(start).TotalMilliseconds;

    /// <summary>Median, P95 and largest of milliseconds.</summary>
    public static string Spread(IReadOnlyCollection<double> values) =>
        FormattableString.Invariant($"P50 {Percentile(values, 50):0.00} ms, P95 {Percentile(values, 95):0.00} ms, largest {values.Max():0.00} ms");

    /// <summary>Where and under what other load: figures without it mean little.</summary>
    public static void PrintMachine()
    {
        const string loadFile = "/proc/loadavg";
        var load = File.Exists(loadFile) ? string.Join(' ', File.ReadAllText(loadFile).Split(' ')[..3]) : "unknown";
        Print($"{Environment.ProcessorCount} cores, {RuntimeInformation.FrameworkDescription}, load average (1, 5, 15 minutes) {load}");
#if DEBUG
        Print($"This is a debug build: its figures mean nothing. Run it with -c Release.");
#endif
    }

    public static void Print(FormattableString line) => Console.WriteLine(FormattableString.Invariant(line));
}
