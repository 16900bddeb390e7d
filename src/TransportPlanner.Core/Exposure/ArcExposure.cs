namespace TransportPlanner.Core.Exposure;

/// <summary>The three figures of a crossing or of a way. They are shown apart; they add up over crossings.</summary>
/// <param name="SharedAirMinutes">Person-minutes in the reference place.</param>
/// <param name="CloseByMinutes">Person-minutes within 2 m.</param>
/// <param name="Touches">Handles and buttons touched by anyone but the clean helper.</param>
public readonly record struct ExposureFigures(double SharedAirMinutes, double CloseByMinutes, int Touches)
{
    public static ExposureFigures operator +(ExposureFigures a, ExposureFigures b) =>
        new(a.SharedAirMinutes + b.SharedAirMinutes, a.CloseByMinutes + b.CloseByMinutes, a.Touches + b.Touches);
}

/// <summary>Exposure of one arc.</summary>
/// <param name="NobodyHeld">By which ways are ranked.</param>
/// <param name="IfPostsHold">The second figure: held places count nobody during, and who comes after hold and airing.</param>
/// <param name="People">Mean number of people in the place; 0 for an end room. A way counts each place once.</param>
/// <param name="TouchPoints">Handles, plates and buttons on the arc, whoever touches them.</param>
/// <param name="OpenDoorMinutes">Part of the shared air that the open door of a positive room of departure lets into the next place.</param>
public readonly record struct ArcExposure(
    ExposureFigures NobodyHeld, ExposureFigures IfPostsHold, double People, int TouchPoints, double OpenDoorMinutes);
