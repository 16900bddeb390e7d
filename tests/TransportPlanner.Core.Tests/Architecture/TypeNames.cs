using System.Collections.Immutable;
using System.Reflection.Metadata;

namespace TransportPlanner.Core.Tests.Architecture;

/// <summary>Reads a signature as the names of all types in it.</summary>
internal sealed class TypeNames : ISignatureTypeProvider<IEnumerable<TypeName>, object?>
{
    public static TypeName Of(MetadataReader reader, TypeDefinitionHandle handle)
    {
        var type = reader.GetTypeDefinition(handle);
        var name = reader.GetString(type.Name);
        if (!type.IsNested)
        {
            return new(reader.GetString(type.Namespace), name);
        }

        var outer = Of(reader, type.GetDeclaringType());
        return outer with { Name = $"{outer.Name}+{name}" };
    }

    public static TypeName Of(MetadataReader reader, TypeReferenceHandle handle)
    {
        var type = reader.GetTypeReference(handle);
        var name = reader.GetString(type.Name);
        if (type.ResolutionScope.Kind != HandleKind.TypeReference)
        {
            return new(reader.GetString(type.Namespace), name);
        }

        var outer = Of(reader, (TypeReferenceHandle)type.ResolutionScope);
        return outer with { Name = $"{outer.Name}+{name}" };
    }

    public IEnumerable<TypeName> GetTypeFromDefinition(MetadataReader reader, TypeDefinitionHandle handle, byte rawTypeKind) => [Of(reader, handle)];

    public IEnumerable<TypeName> GetTypeFromReference(MetadataReader reader, TypeReferenceHandle handle, byte rawTypeKind) => [Of(reader, handle)];

    public IEnumerable<TypeName> GetTypeFromSpecification(MetadataReader reader, object? context, TypeSpecificationHandle handle, byte rawTypeKind) =>
        reader.GetTypeSpecification(handle).DecodeSignature(this, context);

    public IEnumerable<TypeName> GetFunctionPointerType(MethodSignature<IEnumerable<TypeName>> signature) =>
        signature.ParameterTypes.Append(signature.ReturnType).SelectMany(names => names);

    public IEnumerable<TypeName> GetGenericInstantiation(IEnumerable<TypeName> genericType, ImmutableArray<IEnumerable<TypeName>> typeArguments) =>
        genericType.Concat(typeArguments.SelectMany(names => names));

    public IEnumerable<TypeName> GetModifiedType(IEnumerable<TypeName> modifier, IEnumerable<TypeName> unmodifiedType, bool isRequired) =>
        modifier.Concat(unmodifiedType);

    public IEnumerable<TypeName> GetArrayType(IEnumerable<TypeName> elementType, ArrayShape shape) => elementType;

    public IEnumerable<TypeName> GetByReferenceType(IEnumerable<TypeName> elementType) => elementType;

    public IEnumerable<TypeName> GetPinnedType(IEnumerable<TypeName> elementType) => elementType;

    public IEnumerable<TypeName> GetPointerType(IEnumerable<TypeName> elementType) => elementType;

    public IEnumerable<TypeName> GetSZArrayType(IEnumerable<TypeName> elementType) => elementType;

    public IEnumerable<TypeName> GetGenericMethodParameter(object? context, int index) => [];

    public IEnumerable<TypeName> GetGenericTypeParameter(object? context, int index) => [];

    public IEnumerable<TypeName> GetPrimitiveType(PrimitiveTypeCode typeCode) => [];
}
