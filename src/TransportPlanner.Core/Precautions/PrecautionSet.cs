namespace TransportPlanner.Core.Precautions;

/// <summary>Transmission-based precautions in force, as infection prevention entered them; never inferred from a diagnosis.</summary>
[Flags]
public enum PrecautionSet
{
    None = 0,
    Contact = 1,
    Droplet = 2,
    Airborne = 4,
}
