using System.Reflection;
using System.Reflection.Emit;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;

namespace TransportPlanner.Core.Tests.Architecture;

/// <summary>Finds the types that each type of an assembly names, as <see cref="CompiledAssembly"/> describes.</summary>
internal sealed class AssemblyReader : IDisposable
{
    private static readonly Dictionary<int, OperandType> Operands = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(field => (OpCode)field.GetValue(null)!)
        .ToDictionary(code => (int)(ushort)code.Value, code => code.OperandType);

    private readonly PEReader _file;
    private readonly MetadataReader _metadata;
    private readonly TypeNames _names = new();

    public AssemblyReader(string path)
    {
        _file = new(File.OpenRead(path));
        _metadata = _file.GetMetadataReader();
    }

    public IEnumerable<string> References =>
        _metadata.AssemblyReferences.Select(handle => _metadata.GetString(_metadata.GetAssemblyReference(handle).Name));

    public IEnumerable<TypeUse> Uses => UsesOf(_ => true, _ => true, withBodies: true);

    public IEnumerable<TypeUse> PublicSignatureUses => UsesOf(IsVisible, IsVisible, withBodies: false);

    public void Dispose() => _file.Dispose();

    private IEnumerable<TypeUse> UsesOf(Func<TypeDefinition, bool> types, Func<MethodAttributes, bool> members, bool withBodies) =>
        from handle in _metadata.TypeDefinitions
        let type = _metadata.GetTypeDefinition(handle)
        where types(type)
        let user = TypeNames.Of(_metadata, handle)
        from used in TypesNamedBy(type, members, withBodies).Distinct()
        where used != user
        select new TypeUse(user, used);

    private bool IsVisible(TypeDefinition type) => (type.Attributes & TypeAttributes.VisibilityMask) switch
    {
        TypeAttributes.Public => true,
        TypeAttributes.NestedPublic or TypeAttributes.NestedFamily => IsVisible(_metadata.GetTypeDefinition(type.GetDeclaringType())),
        _ => false,
    };

    // Fields and methods code their access in the same bits.
    private static bool IsVisible(MethodAttributes member) =>
        (member & MethodAttributes.MemberAccessMask) is MethodAttributes.Public or MethodAttributes.Family or MethodAttributes.FamORAssem;

    private IEnumerable<TypeName> TypesNamedBy(TypeDefinition type, Func<MethodAttributes, bool> members, bool withBodies)
    {
        var bases = type.GetInterfaceImplementations().Select(i => _metadata.GetInterfaceImplementation(i).Interface).Append(type.BaseType);
        var bounds = type.GetGenericParameters().SelectMany(BoundsOf);
        var fields = type.GetFields().Select(_metadata.GetFieldDefinition).Where(field => members((MethodAttributes)field.Attributes));
        var methods = type.GetMethods().Select(_metadata.GetMethodDefinition).Where(method => members(method.Attributes)).ToList();
        return bases.Concat(bounds).SelectMany(NamedBy)
            .Concat(fields.SelectMany(field => field.DecodeSignature(_names, null)))
            .Concat(methods.SelectMany(method => NamesIn(method.DecodeSignature(_names, null))))
            .Concat(methods.SelectMany(method => method.GetGenericParameters().SelectMany(BoundsOf).SelectMany(NamedBy)))
            .Concat(withBodies ? methods.SelectMany(NamedInBody).Concat(type.GetCustomAttributes().SelectMany(attribute => NamedBy(attribute))) : []);
    }

    private IEnumerable<EntityHandle> BoundsOf(GenericParameterHandle parameter) =>
        _metadata.GetGenericParameter(parameter).GetConstraints().Select(bound => _metadata.GetGenericParameterConstraint(bound).Type);

    private IEnumerable<TypeName> NamedInBody(MethodDefinition method)
    {
        if (method.RelativeVirtualAddress == 0)
        {
            return [];
        }

        var body = _file.GetMethodBody(method.RelativeVirtualAddress);
        var locals = body.LocalSignature.IsNil ? [] : _metadata.GetStandaloneSignature(body.LocalSignature).DecodeLocalSignature(_names, null);
        return locals.SelectMany(names => names)
            .Concat(body.ExceptionRegions.SelectMany(region => NamedBy(region.CatchType)))
            .Concat(TokensIn(body.GetILReader()).SelectMany(NamedBy));
    }

    private static List<EntityHandle> TokensIn(BlobReader code)
    {
        var tokens = new List<EntityHandle>();
        while (code.RemainingBytes > 0)
        {
            int operation = code.ReadByte();
            if (operation == 0xFE)
            {
                operation = 0xFE00 | code.ReadByte();
            }

            switch (Operands[operation])
            {
                case OperandType.InlineField or OperandType.InlineMethod or OperandType.InlineTok or OperandType.InlineType:
                    tokens.Add(MetadataTokens.EntityHandle(code.ReadInt32()));
                    break;
                case OperandType.InlineSwitch:
                    var targets = code.ReadInt32();
                    code.Offset += 4 * targets;
                    break;
                case OperandType.InlineNone:
                    break;
                case OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar:
                    code.Offset += 1;
                    break;
                case OperandType.InlineVar:
                    code.Offset += 2;
                    break;
                case OperandType.InlineI8 or OperandType.InlineR:
                    code.Offset += 8;
                    break;
                default:
                    code.Offset += 4;
                    break;
            }
        }

        return tokens;
    }

    private IEnumerable<TypeName> NamedBy(EntityHandle handle)
    {
        if (handle.IsNil)
        {
            return [];
        }

        switch (handle.Kind)
        {
            case HandleKind.TypeDefinition:
                return [TypeNames.Of(_metadata, (TypeDefinitionHandle)handle)];
            case HandleKind.TypeReference:
                return [TypeNames.Of(_metadata, (TypeReferenceHandle)handle)];
            case HandleKind.TypeSpecification:
                return _metadata.GetTypeSpecification((TypeSpecificationHandle)handle).DecodeSignature(_names, null);
            case HandleKind.FieldDefinition:
                var field = _metadata.GetFieldDefinition((FieldDefinitionHandle)handle);
                return field.DecodeSignature(_names, null).Concat(NamedBy(field.GetDeclaringType()));
            case HandleKind.MethodDefinition:
                var method = _metadata.GetMethodDefinition((MethodDefinitionHandle)handle);
                return NamesIn(method.DecodeSignature(_names, null)).Concat(NamedBy(method.GetDeclaringType()));
            case HandleKind.MethodSpecification:
                var instance = _metadata.GetMethodSpecification((MethodSpecificationHandle)handle);
                return instance.DecodeSignature(_names, null).SelectMany(names => names).Concat(NamedBy(instance.Method));
            case HandleKind.MemberReference:
                var member = _metadata.GetMemberReference((MemberReferenceHandle)handle);
                var signature = member.GetKind() == MemberReferenceKind.Field
                    ? member.DecodeFieldSignature(_names, null)
                    : NamesIn(member.DecodeMethodSignature(_names, null));
                return signature.Concat(NamedBy(member.Parent));
            case HandleKind.CustomAttribute:
                return NamedBy(_metadata.GetCustomAttribute((CustomAttributeHandle)handle).Constructor);
            default:
                throw new NotSupportedException($"A type is not named by a {handle.Kind}.");
        }
    }

    private static IEnumerable<TypeName> NamesIn(MethodSignature<IEnumerable<TypeName>> signature) =>
        signature.ParameterTypes.Append(signature.ReturnType).SelectMany(names => names);
}
