namespace TransportPlanner.Core.Gas;

/// <summary>A gas in a cylinder whose amount follows its pressure.</summary>
public enum GasKind
{
    Oxygen,
    /// <summary>Medical air.</summary>
    Air,
}
