namespace TransportPlanner.Core.Gas;

/// <summary>Where the air of a blend comes from.</summary>
public enum AirSource
{
    /// <summary>Air cylinders; none given counts as zero minutes.</summary>
    Cylinder,
    /// <summary>A compressor that travels along.</summary>
    Compressor,
    /// <summary>Room air drawn in by the device.</summary>
    Entrained,
}
