namespace TransportPlanner.Core.FloorPlans;

/// <summary>How a fact about the building is known.</summary>
public enum FactSource
{
    /// <summary>Taken for granted until somebody looks: shown with the word <i>assumed</i>.</summary>
    Assumed,
    /// <summary>Read from a drawing, a handover file or a design schedule.</summary>
    Drawing,
    /// <summary>Measured on site.</summary>
    Measured,
}

/// <summary>One fact about the building with how and when it became known. Default: <see cref="Fact.Unknown{T}"/>, which is a value and never a zero.</summary>
/// <remarks>A check that needs an unknown fact answers <i>unknown</i>, never <i>passed</i>.</remarks>
public readonly record struct Fact<T>
    where T : struct
{
    private readonly T _value;

    public Fact(T value, FactSource source, DateOnly? asOf = null) => (_value, Source, AsOf, IsKnown) = (value, source, asOf, true);

    public bool IsKnown { get; }
    public FactSource Source { get; }

    /// <summary>Day of the measurement, of the drawing's issue, or of the assumption; null when nobody wrote it down.</summary>
    public DateOnly? AsOf { get; }

    /// <exception cref="InvalidOperationException">The fact is unknown; ask <see cref="IsKnown"/> first.</exception>
    public T Value => IsKnown ? _value : throw new InvalidOperationException("The fact is unknown.");

    public T? OrNull => IsKnown ? _value : null;
    public T Or(T assumed) => IsKnown ? _value : assumed;

    public override string ToString() => IsKnown ? FormattableString.Invariant($"{_value} ({Source})") : "unknown";
}

/// <summary>Short ways to write a fact down.</summary>
public static class Fact
{
    public static Fact<T> Unknown<T>() where T : struct => default;
    public static Fact<T> Measured<T>(T value, DateOnly? asOf = null) where T : struct => new(value, FactSource.Measured, asOf);
    public static Fact<T> Drawing<T>(T value, DateOnly? asOf = null) where T : struct => new(value, FactSource.Drawing, asOf);
    public static Fact<T> Assumed<T>(T value, DateOnly? asOf = null) where T : struct => new(value, FactSource.Assumed, asOf);
}
