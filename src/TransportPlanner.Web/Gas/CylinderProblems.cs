using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Gas;

/// <summary>Why a cylinder of a well-formed request is refused; every code comes with 422 and the path of sizeId.</summary>
internal enum CylinderProblemCode
{
    /// <summary>A letter means different cylinders in different countries; candidates lists them with their litres.</summary>
    SizeWithoutCountry,
    /// <summary>The id is not in the cylinder library.</summary>
    UnknownSize,
    /// <summary>The size is listed for another gas; contents of one gas are never used for another.</summary>
    SizeOfOtherGas,
    /// <summary>The library knows the litres of this size but not the pressure of a full cylinder, so a gauge reading says nothing.</summary>
    SizeWithoutPressure,
    /// <summary>The site entered the size once, and no second role confirmed it.</summary>
    SizeNotConfirmed,
}

/// <summary>Turns the cylinders of a request into those of the computation, or into the problem that says what to give instead.</summary>
internal static class CylinderProblems
{
    /// <param name="requests">Validated cylinders of a request body.</param>
    /// <param name="path">CamelCase path of the list in the body.</param>
    /// <param name="choice">What they may be.</param>
    /// <param name="cylinders">The cylinders where null is returned; else empty.</param>
    public static ProblemHttpResult? Find(IReadOnlyList<CylinderRequest> requests, string path, CylinderChoice choice, out IReadOnlyList<Cylinder> cylinders)
    {
        cylinders = [];
        var answers = requests.Select(request => request.Find(choice)).ToList();
        var refused = answers.Index().Where(pair => pair.Item is CylinderAnswer.Refused).ToDictionary(
            pair => $"{path}[{pair.Index}].{JsonErrors.CamelCase(((CylinderAnswer.Refused)pair.Item).Member)}", pair => new[] { ((CylinderAnswer.Refused)pair.Item).Words });
        if (refused.Count > 0)
            return Problems.Invalid(refused);
        foreach (var (i, answer) in answers.Index())
        {
            if (answer is CylinderAnswer.NoSize no)
                return Refuse(no, $"{path}[{i}].sizeId");
        }

        cylinders = [.. answers.Cast<CylinderAnswer.Found>().Select(found => found.Cylinder)];
        return null;
    }

    private static ProblemHttpResult Refuse(CylinderAnswer.NoSize no, string path) => no.Lookup switch
    {
        CylinderLookup.NoCountry letter => Problems.Impossible(
            CylinderProblemCode.SizeWithoutCountry, $"{no}", ("errors", new Dictionary<string, string[]> { [path] = [$"{no}"] }),
            ("candidates", letter.Candidates.Select(CylinderSizeResponse.From))),
        CylinderLookup.OtherGas => Problems.ImpossibleField(CylinderProblemCode.SizeOfOtherGas, path, $"{no}"),
        CylinderLookup.NoPressure => Problems.ImpossibleField(CylinderProblemCode.SizeWithoutPressure, path, $"{no}"),
        CylinderLookup.NotConfirmed => Problems.ImpossibleField(CylinderProblemCode.SizeNotConfirmed, path, $"{no}"),
        CylinderLookup.Unknown => Problems.ImpossibleField(CylinderProblemCode.UnknownSize, path, $"{no}"),
        _ => throw new InvalidOperationException($"No problem for {no}."),
    };
}
