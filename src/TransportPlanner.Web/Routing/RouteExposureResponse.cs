using TransportPlanner.Core.Exposure;

namespace TransportPlanner.Web.Routing;

/// <summary>The terms of exposure, with nobody held. They compare ways; they predict nothing about a person.</summary>
/// <param name="SharedAirMinutes">Person-minutes in a reference place that receives 300 m³/h of clean air.</param>
/// <param name="CloseByMinutes">Person-minutes within 2 m.</param>
/// <param name="Touches">Handles, plates and buttons touched by anyone but the clean helper.</param>
/// <param name="IfPostsHold">The same with every held place empty.</param>
public sealed record RouteExposureResponse(double SharedAirMinutes, double CloseByMinutes, int Touches, ExposureIfPostsHoldResponse IfPostsHold)
{
    internal static RouteExposureResponse From(ExposureFigures open, ExposureFigures held) => new(
        Math.Round(open.SharedAirMinutes, 3), Math.Round(open.CloseByMinutes, 3), open.Touches,
        new(Math.Round(held.SharedAirMinutes, 3), Math.Round(held.CloseByMinutes, 3), held.Touches));
}

/// <summary>The terms of exposure when every post holds.</summary>
/// <param name="SharedAirMinutes">Person-minutes in a reference place that receives 300 m³/h of clean air.</param>
/// <param name="CloseByMinutes">Person-minutes within 2 m.</param>
/// <param name="Touches">Handles, plates and buttons touched by anyone but the clean helper.</param>
public sealed record ExposureIfPostsHoldResponse(double SharedAirMinutes, double CloseByMinutes, int Touches);
